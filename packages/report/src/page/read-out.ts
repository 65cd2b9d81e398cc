/**
 * The report's only script: points to the nearest post as the pointer or the arrow keys move over a figure and reads
 * its numbers out below. Without it every post still has its numbers as a title, and the tables hold them all.
 */
export const readOutScript = `(()=>{
for(const group of document.querySelectorAll('figure .hits')){
const svg=group.closest('svg'),hits=[...group.children];
if(!hits.length)continue;
const read=document.createElement('p'),both=group.dataset.near==='xy';
read.className='read';
read.setAttribute('role','status');
read.textContent=matchMedia('(hover:none)').matches?'Touch the drawing to read out a post.':'Point at a post to read it out, or select the drawing and use the arrow keys.';
svg.after(read);
const words=hits.map(hit=>{const title=hit.querySelector('title'),text=title.textContent;title.remove();return text});
const middles=hits.map(hit=>{const box=hit.getBBox();return[box.x+box.width/2,box.y+box.height/2]});
let now=-1;
const show=i=>{if(i===now)return;if(now>=0)hits[now].classList.remove('on');now=i;hits[i].classList.add('on');read.textContent=words[i]};
const find=event=>{
const at=new DOMPoint(event.clientX,event.clientY).matrixTransform(group.getScreenCTM().inverse());
let best=0,least=Infinity;
middles.forEach(([x,y],i)=>{const far=both?Math.hypot(x-at.x,y-at.y):Math.abs(x-at.x);if(far<least){least=far;best=i}});
show(best)};
svg.addEventListener('pointermove',find);
svg.addEventListener('pointerdown',find);
svg.setAttribute('tabindex','0');
svg.addEventListener('keydown',event=>{
const step={ArrowRight:1,ArrowDown:1,ArrowLeft:-1,ArrowUp:-1}[event.key];
if(step)show(Math.max(0,Math.min(hits.length-1,now+step)));
else if(event.key==='Home')show(0);
else if(event.key==='End')show(hits.length-1);
else return;
event.preventDefault()});
}})();`;
